"""What kind of goods?  A category may be a path "A > B": first part top, last part sub; one level is both."""


def plain_path(category: str) -> str:
    """A path in one spelling: lower case, single spaces, " > " between its parts; "" for blank.

    Examples
    --------
    >>> plain_path(" Home>Kitchen  tools "), plain_path("TOYS"), plain_path("")
    ('home > kitchen tools', 'toys', '')
    """
    parts = [" ".join(part.lower().split()) for part in category.split(">")]
    return " > ".join(part for part in parts if part)


def top_and_sub(category: str) -> tuple[str, str]:
    """First and last part of a path, lower case with single spaces; both "" for blank.

    Examples
    --------
    >>> top_and_sub("Home > Kitchen > Mixers"), top_and_sub(" Toys "), top_and_sub("")
    (('home', 'mixers'), ('toys', 'toys'), ('', ''))
    """
    parts = [" ".join(part.lower().split()) for part in category.split(">")]
    parts = [part for part in parts if part] or [""]
    return parts[0], parts[-1]
