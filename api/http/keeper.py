"""Whom do we know?  The door's question to the store."""

from api.http.middleware.visitors import Credentials, Doorkeeper, Visitor
from models.services.environment import Environment
from models.services.secret import form_token
from models.services.sign_in import session_caller
from models.services.tokens import token_caller
from models.store.unit_of_work import Store
from models.values.errors import NotSignedIn


def keeper(environment: Environment, store: Store) -> Doorkeeper:
    """A look-up in a short transaction of its own, over before the body is read."""
    key = environment.secret_key.get_secret_value()

    def look_up(credentials: Credentials) -> Visitor | None:
        with store.read() as work:
            try:
                if credentials.token:
                    caller = token_caller(work, credentials.token)
                else:
                    caller = session_caller(work, credentials.session)
            except NotSignedIn:
                return None
            proof = form_token(key, credentials.session) if credentials.session else ""
            return Visitor(caller, work.shops.require(caller.shop), proof)

    return look_up
