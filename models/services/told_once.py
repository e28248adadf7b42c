"""Say a lasting trouble once, not at every try; and say when it is over."""

import logging


class ToldOnce:
    """One trouble of one process; `over` where the same thing has just worked."""

    def __init__(self, log: logging.Logger) -> None:
        self._log = log
        self._told = ""

    def say(self, message: str) -> None:
        """Log it, unless it was the last thing said."""
        if message != self._told:
            self._told = message
            self._log.error(message)

    def over(self) -> None:
        """It works again."""
        if self._told:
            self._told = ""
            self._log.warning("That is over: work goes on.")
