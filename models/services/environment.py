"""What does the machine tell the service?  Read once at an entry point; the README's table is made from it."""

import os
import secrets
from dataclasses import fields
from pathlib import Path
from typing import Any

from pydantic import Field, SecretStr
from pydantic_settings import BaseSettings, SettingsConfigDict

from models.intake.limits import Limits

_READ = {limit.name: limit for limit in fields(Limits)}


def _of_reading(name: str) -> Any:
    """A limit for reading one file, declared where it is kept; `models/intake/confined.py` hands it to its child."""
    limit = _READ[name]
    return Field(limit.default, ge=limit.metadata["lowest"], description=limit.metadata["meaning"])


class Environment(BaseSettings):
    """Environment variables, each with the prefix LOTWRIGHT_."""

    model_config = SettingsConfigDict(env_prefix="LOTWRIGHT_", extra="ignore")

    data_dir: Path = Field(Path("lotwright-data"), description="Folder of the database, the queue and the secret key.")
    database_url: str = Field(
        "", description="Database; empty: SQLite in the data folder. PostgreSQL: postgresql+psycopg://..."
    )
    broker_url: str = Field("", description="Queue; empty: SQLite in the data folder. Redis: redis://host:6379/0")
    secret_key: SecretStr = Field(
        SecretStr(""), description="Key that signs form tokens; empty: made once and kept in the data folder."
    )
    max_upload_mib: int = Field(64, ge=1, le=4096, description="Largest file accepted [MiB].")
    max_uncompressed_mib: int = _of_reading("max_uncompressed_mib")
    max_rows: int = _of_reading("max_rows")
    max_columns: int = _of_reading("max_columns")
    max_cells: int = _of_reading("max_cells")
    max_cell_characters: int = _of_reading("max_cell_characters")
    max_read_mib: int = _of_reading("max_read_mib")
    max_read_cpu_seconds: int = _of_reading("max_read_cpu_seconds")
    max_read_seconds: int = _of_reading("max_read_seconds")
    chromium: str = Field("", description="Chromium program for PDF reports; empty: looked for on the path.")
    public_url: str = Field(
        "", description="Address people reach the service at, for links; empty: the address it listens on."
    )
    session_days: int = Field(30, ge=1, le=365, description="Days until a sign-in expires.")
    job_days: int = Field(90, ge=1, description="Days that finished jobs are kept.")
    upload_days: int = Field(
        365, ge=1, description="Days that uploaded files are kept; sales, lots and evaluations stay."
    )

    @property
    def embedded(self) -> bool:
        """True where the queue is a file of this machine, so that `serve` starts its own workers."""
        return self.broker.startswith("sqla+")

    @property
    def database(self) -> str:
        """The database's address."""
        return self.database_url or f"sqlite:///{self.data_dir.resolve() / 'lotwright.db'}"

    @property
    def broker(self) -> str:
        """The queue's address."""
        return self.broker_url or f"sqla+sqlite:///{self.broker_file}"

    @property
    def broker_file(self) -> Path:
        """The queue's file in embedded mode; it holds wake-ups only, so `serve` starts with a fresh one."""
        return self.data_dir.resolve() / "queue.db"

    @property
    def open_to_others(self) -> bool:
        """True if other users of this machine can look into the data folder."""
        return os.name == "posix" and bool(self.data_dir.stat().st_mode & 0o055)

    @property
    def max_upload_bytes(self) -> int:
        """Largest file accepted [bytes]."""
        return self.max_upload_mib * 1024 * 1024


def load_environment(**given: Any) -> Environment:
    """The environment with its data folder and secret key in place; `given` goes before the variables."""
    environment = Environment(**{name: value for name, value in given.items() if value is not None})
    environment.data_dir.mkdir(mode=0o700, parents=True, exist_ok=True)
    if environment.secret_key.get_secret_value():
        return environment
    return environment.model_copy(update={"secret_key": SecretStr(_kept_key(environment.data_dir / "secret.key"))})


def _kept_key(file: Path) -> str:
    """The key in `file`; made there, readable by its owner only, if it is not there yet."""
    try:
        descriptor = os.open(file, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    except FileExistsError:
        return file.read_text().strip()
    with os.fdopen(descriptor, "w") as made:
        made.write(secrets.token_hex(32))
    return file.read_text().strip()
