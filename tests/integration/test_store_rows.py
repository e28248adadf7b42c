"""Shops, people, settings, files: what the services of these promise, on both databases."""

import time

import pytest

from models.services.idempotency import get_answer, keep_answer, request_fingerprint
from models.services.prune import ANSWER_DAYS
from models.services.secret import hashed
from models.services.shop_settings import put_settings, put_source_settings, read_settings, read_sources
from models.services.sign_in import create_sign_in_link, redeem_sign_in_link, session_caller, sign_out
from models.services.submit_import import submit_import
from models.services.submit_lot import LotAsked, submit_lot
from models.services.tokens import create_token, read_tokens, revoke_token, token_caller
from models.services.users import add_user, get_first_owner, open_shop, require_member
from models.store.queries.blobs import CHUNK_BYTES, Blobs
from models.store.records import ShopId, Upload
from models.store.states import Role
from models.store.unit_of_work import Store
from models.values.errors import Conflict, NotFound, NotSignedIn, Rejected, StaleVersion


def test_the_first_user_owns_the_first_shop(store: Store) -> None:
    with store.write() as work:
        assert get_first_owner(work) is None
        first = add_user(work, " Seller@Example.org ")
        second = add_user(work, "helper@example.org")
    with store.read() as work:
        assert get_first_owner(work) == first
        assert (first.role, second.role, second.shop) == (Role.OWNER, Role.MEMBER, first.shop)
        assert require_member(work, "SELLER@example.org") == first
    with pytest.raises(Conflict), store.write() as work:
        add_user(work, "seller@example.org")
    with pytest.raises(Rejected), store.write() as work:
        add_user(work, "no address")
    with pytest.raises(NotFound), store.read() as work:
        require_member(work, "nobody@example.org")


@pytest.mark.parametrize(("zone", "currency"), [("Mars/Base", "USD"), ("UTC", "usd")])
def test_a_shop_has_a_real_zone_and_currency(store: Store, zone: str, currency: str) -> None:
    with pytest.raises(Rejected), store.write() as work:
        open_shop(work, "Shop", zone, currency)


def test_a_sign_in_link_is_good_once(store: Store) -> None:
    with store.write() as work:
        member = add_user(work, "a@example.org")
        secret = create_sign_in_link(work, "a@example.org")
    with store.write() as work:
        session = redeem_sign_in_link(work, secret)
    assert (session.caller.shop, session.caller.role, session.caller.via) == (member.shop.id, Role.OWNER, "session")
    with pytest.raises(NotSignedIn), store.write() as work:
        redeem_sign_in_link(work, secret)
    with store.write() as work:
        assert session_caller(work, session.secret) == session.caller
        sign_out(work, session.secret)
    with pytest.raises(NotSignedIn), store.read() as work:
        session_caller(work, session.secret)


def test_links_and_sessions_expire(store: Store) -> None:
    with store.write() as work:
        user = add_user(work, "a@example.org").user
        late = create_sign_in_link(work, "a@example.org", minutes=0)
        work.people.add_session(user.id, hashed("short"), 1)
    time.sleep(0.01)
    with pytest.raises(NotSignedIn), store.write() as work:
        redeem_sign_in_link(work, late)
    with pytest.raises(NotSignedIn), store.read() as work:
        session_caller(work, "short")
    with store.write() as work:
        assert work.people.prune() == 2


def test_a_token_is_kept_as_a_hash_and_can_be_revoked(store: Store) -> None:
    with store.write() as work:
        member = add_user(work, "a@example.org")
        with pytest.raises(Rejected, match="needs a name"):
            create_token(work, member.shop.id, member.user.id, " \t")
        made = create_token(work, member.shop.id, member.user.id, "script")
        other = open_shop(work, "Other").id
    with store.write() as work:
        assert token_caller(work, made.secret).email == "a@example.org"
        assert read_tokens(work, member.shop.id) == (made.token,)
        assert read_tokens(work, other) == ()
        with pytest.raises(NotFound):
            revoke_token(work, other, made.token.id)
        revoke_token(work, member.shop.id, made.token.id)
        with pytest.raises(NotSignedIn):
            token_caller(work, made.secret)


def test_settings_are_replaced_only_by_who_read_them(store: Store, shop: ShopId) -> None:
    with store.write() as work:
        before = read_settings(work, shop)
        after = put_settings(work, shop, {"buying": {"premium": 0.1}}, before.version)
    assert (before.version, after.version, after.given) == (1, 2, {"buying": {"premium": 0.1}})
    assert "premium" not in after.assumed["buying"]
    assert before.assumed["buying"]["premium"] == 0.15
    with pytest.raises(StaleVersion), store.write() as work:
        put_settings(work, shop, {}, before.version)
    with pytest.raises(Rejected), store.write() as work:
        put_settings(work, shop, {"buying": {"premium": 7}}, 2)


def test_a_currency_is_fixed_once_amounts_are_stored(store: Store, shop: ShopId) -> None:
    with store.write() as work:
        put_settings(work, shop, {"currency": "EUR"}, 1)
        assert work.shops.require(shop).currency == "EUR"
        submit_import(work, shop, Upload("h.csv", [b"x"]))
    with pytest.raises(Conflict), store.write() as work:
        put_settings(work, shop, {"currency": "JPY"}, 2)
    with pytest.raises(Rejected), store.write() as work:
        submit_lot(work, shop, Upload("m.csv", [b"x"]), LotAsked("Lot", {"currency": "USD"}))


def test_a_source_keeps_its_terms(store: Store, shop: ShopId) -> None:
    with store.write() as work:
        submit_lot(work, shop, Upload("m.csv", [b"x"]), LotAsked("Lot", {"lot": {"source": "North hall"}}))
        put_source_settings(work, shop, "North hall", {"buying": {"premium": 0.2}}, 1)
        assert [(one.name, one.version) for one in read_sources(work, shop)] == [("North hall", 2)]
        lot = submit_lot(work, shop, Upload("m.csv", [b"x"]), LotAsked("Lot", {"lot": {"source": "North hall"}}))
    with store.write() as work:
        payload = work.claims.claim_next(lot.job.queue)
        assert payload is not None
        payload = work.claims.claim_next(lot.job.queue)
        assert payload is not None
        assert payload.payload["given"][1] == {"buying": {"premium": 0.2}}
    with pytest.raises(StaleVersion), store.write() as work:
        put_source_settings(work, shop, "North hall", {}, 1)


def test_bytes_come_back_in_checked_chunks(store: Store, shop: ShopId) -> None:
    content = bytes(range(256)) * (CHUNK_BYTES // 100)
    parts = [content[:7], content[7:CHUNK_BYTES], b"", content[CHUNK_BYTES:]]
    with store.write() as work:
        upload = work.uploads.add(shop, Upload("big.bin", parts))
        other = open_shop(work, "Other").id
    assert upload.size == len(content)
    with store.read() as work:
        assert work.uploads.content(shop, upload.id) == content
        with pytest.raises(NotFound):
            work.uploads.require(other, upload.id)


def test_a_damaged_chunk_is_noticed(store: Store, shop: ShopId) -> None:
    with store.write() as work:
        blob_id, _, _ = Blobs(work._connection).add(shop, [b"content"])
        work._connection.exec_driver_sql(f"UPDATE chunk SET sha256 = 'x' WHERE blob_id = '{blob_id}'")
        with pytest.raises(OSError, match="damaged"):
            Blobs(work._connection).read(shop, blob_id)
        work._connection.exec_driver_sql(f"DELETE FROM chunk WHERE blob_id = '{blob_id}'")
        with pytest.raises(OSError, match="missing"):
            Blobs(work._connection).read(shop, blob_id)


def test_pruned_files_say_so(store: Store, shop: ShopId) -> None:
    with store.write() as work:
        upload = work.uploads.add(shop, Upload("a.csv", [b"x"]))
    time.sleep(0.01)
    with store.write() as work:
        assert work.uploads.prune(1) == 1
        assert work.uploads.prune(1) == 0
    with pytest.raises(Conflict), store.read() as work:
        work.uploads.content(shop, upload.id)


def test_a_file_name_is_made_storable(store: Store, shop: ShopId) -> None:
    with store.write() as work:
        assert work.uploads.add(shop, Upload("a\0b\ud800\n.csv", [b"x"])).filename == "ab.csv"
        lot = submit_lot(work, shop, Upload("m.csv", [b"x"]), LotAsked(" A\0 lot\n "))
    assert lot.subject.name == "A lot"


def test_an_idempotency_key_answers_one_request_once(store: Store, shop: ShopId) -> None:
    one, two = request_fingerprint("POST", "/lots", b"a"), request_fingerprint("POST", "/lots", b"b")
    with store.write() as work:
        assert get_answer(work, shop, "key", one) is None
        keep_answer(work, shop, "key", one, 202, {"lot": "1"})
        other = open_shop(work, "Other").id
    with store.read() as work:
        answer = get_answer(work, shop, "key", one)
        assert answer is not None
        assert (answer.status, answer.body) == (202, {"lot": "1"})
        assert get_answer(work, other, "key", two) is None
        with pytest.raises(Conflict):
            get_answer(work, shop, "key", two)
    with pytest.raises(Conflict), store.write() as work:
        keep_answer(work, shop, "key", one, 202, {})
    with store.write() as work:
        assert work.answers.prune(ANSWER_DAYS * 24 * 3600 * 1000) == 0
        assert work.answers.prune(-1000) == 1
