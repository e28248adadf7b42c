"""What `lotwright user add` says to do next."""

from api.cli.user import what_next


def test_an_address_is_whole_and_what_may_be_missing_is_said() -> None:
    said = what_next("", "/sign-in/link_x")
    assert said[0] == "Sign in once, within an hour: http://127.0.0.1:8000/sign-in/link_x"
    assert "`lotwright serve`" in said[1]
    assert "LOTWRIGHT_PUBLIC_URL" in said[2]


def test_a_known_address_needs_no_more() -> None:
    said = what_next("https://lots.example/", "/sign-in/link_x")
    assert said[0] == "Sign in once, within an hour: https://lots.example/sign-in/link_x"
    assert len(said) == 2
