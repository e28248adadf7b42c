"""Secrets people and programs show: random, given out once, kept only as a hash."""

import hashlib
import hmac
import secrets


def new_secret(prefix: str) -> str:
    """A fresh secret of 256 random bits; the prefix tells a reader of a leak what it is."""
    return f"{prefix}_{secrets.token_urlsafe(32)}"


def hashed(secret: str) -> str:
    """What is stored.  A plain SHA-256 is enough: 256 random bits cannot be guessed from it."""
    return hashlib.sha256(secret.encode()).hexdigest()


def form_token(secret_key: str, session_secret: str) -> str:
    """The token that a session's forms carry against requests forged by other sites."""
    return hmac.new(secret_key.encode(), session_secret.encode(), hashlib.sha256).hexdigest()


def same_form_token(secret_key: str, session_secret: str, shown: str) -> bool:
    """True if `shown` is this session's form token, compared in constant time."""
    return hmac.compare_digest(form_token(secret_key, session_secret), shown)
