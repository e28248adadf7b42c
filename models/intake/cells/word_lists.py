"""How are lists of words written down in this room?  As texts separated by semicolons, which wrap and read well."""


def word_list(text: str) -> tuple[str, ...]:
    """The words of a list, in order, white space single.

    Examples
    --------
    >>> word_list("open box; like\\n   new")
    ('open box', 'like new')
    """
    return tuple(" ".join(word.split()) for word in text.split(";") if word.strip())
