"""The README says what the product is first, and names every setting as the code declares it."""

from pathlib import Path

from pydantic import SecretStr

from models.services.environment import Environment
from models.values.settings_table import settings_table

README = (Path(__file__).parents[2] / "README.md").read_text()


def test_every_setting_is_in_the_table_made_from_the_registry() -> None:
    table = README.split("<!-- settings table: python -m models.values.settings_table -->\n")[1]
    assert table.split("\n<!-- end of settings table -->")[0] == settings_table()


def test_every_environment_variable_is_told_with_its_default() -> None:
    for name, field in Environment.model_fields.items():
        default = field.default.get_secret_value() if isinstance(field.default, SecretStr) else field.default
        row = f"| `LOTWRIGHT_{name.upper()}` | {default if str(default) else 'empty'} | {field.description} |"
        assert row in README, row


def test_the_job_comes_first_and_two_commands_do_all_their_set_up() -> None:
    first = README.split("\n\n")[1]
    for word in ("manifest", "sold history", "bid ceiling", "hours", "backlog"):
        assert word in first
    commands = [line for line in README.splitlines() if line.startswith("python3 -m venv")]
    assert [command.split()[-1] for command in commands] == ["demo", "-q"]
