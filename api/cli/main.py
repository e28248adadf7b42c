"""The command `lotwright`: one file a command; what computes is imported when it runs, so --help is quick."""

import typer

from api.cli.backtest import backtest
from api.cli.bench import bench
from api.cli.check import check
from api.cli.demo import demo
from api.cli.evaluate import evaluate
from api.cli.migrate import migrate
from api.cli.serve import serve
from api.cli.token import tokens
from api.cli.user import users
from api.cli.worker import worker
from models.services.threads import one_thread

one_thread()  # before anything loads numpy

app = typer.Typer(
    help="The most you can bid for a bulk lot, from your own sold history.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
)
app.command()(demo)
app.command()(serve)
app.command()(evaluate)
app.command()(backtest)
app.command()(bench)
app.command()(worker)
app.command()(migrate)
app.command()(check)
app.add_typer(users, name="user")
app.add_typer(tokens, name="token")

if __name__ == "__main__":
    app()
