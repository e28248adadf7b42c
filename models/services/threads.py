"""One thread for linear algebra.  Two made one fit 3 to 15 times slower: entry points call this before numpy loads."""

import os

_LIMITS = ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS", "BLIS_NUM_THREADS", "VECLIB_MAXIMUM_THREADS")


def one_thread() -> None:
    """Cap every linear algebra library of this process and its children at one thread."""
    os.environ.update(dict.fromkeys(_LIMITS, "1"))
