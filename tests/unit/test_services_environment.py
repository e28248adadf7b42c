"""What the machine tells the service: defaults, the kept key, addresses."""

import stat
from pathlib import Path

import pytest
from pydantic import ValidationError

from models.services.environment import Environment, load_environment


@pytest.fixture(autouse=True)
def _unset(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    for name in Environment.model_fields:
        monkeypatch.delenv(f"LOTWRIGHT_{name.upper()}", raising=False)
    monkeypatch.chdir(tmp_path)


def test_nothing_set_means_sqlite_in_the_data_folder(tmp_path: Path) -> None:
    made = load_environment(data_dir=tmp_path / "kept")
    assert made.database == f"sqlite:///{tmp_path}/kept/lotwright.db"
    assert made.broker == f"sqla+sqlite:///{tmp_path}/kept/queue.db"
    assert made.embedded
    assert made.max_upload_bytes == 64 * 1024 * 1024


def test_two_addresses_make_it_distributed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("LOTWRIGHT_DATA_DIR", str(tmp_path))
    monkeypatch.setenv("LOTWRIGHT_DATABASE_URL", "postgresql+psycopg://db/lotwright")
    monkeypatch.setenv("LOTWRIGHT_BROKER_URL", "redis://queue:6379/0")
    made = load_environment()
    assert (made.database, made.broker) == ("postgresql+psycopg://db/lotwright", "redis://queue:6379/0")
    assert not made.embedded


def test_the_key_is_made_once_and_read_by_its_owner_only(tmp_path: Path) -> None:
    key = load_environment(data_dir=tmp_path).secret_key.get_secret_value()
    assert len(key) == 64
    assert load_environment(data_dir=tmp_path).secret_key.get_secret_value() == key
    assert stat.S_IMODE((tmp_path / "secret.key").stat().st_mode) == 0o600
    assert key not in repr(load_environment(data_dir=tmp_path))


def test_a_given_key_is_not_written_down(tmp_path: Path) -> None:
    assert load_environment(data_dir=tmp_path, secret_key="given").secret_key.get_secret_value() == "given"
    assert not (tmp_path / "secret.key").exists()


@pytest.mark.parametrize("name", ["max_upload_mib", "session_days", "job_days", "upload_days"])
def test_a_number_out_of_reach_is_refused(name: str, tmp_path: Path) -> None:
    with pytest.raises(ValidationError):
        load_environment(data_dir=tmp_path, **{name: 0})


def test_every_variable_is_described() -> None:
    assert all(field.description for field in Environment.model_fields.values())
