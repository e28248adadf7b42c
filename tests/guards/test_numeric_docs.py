"""Every public function of the numeric rooms says what it takes and gives; the long ones state it in numpydoc."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
NUMERIC = ("values", "intake", "estimate", "decide")


def public_functions() -> Iterator[tuple[str, ast.FunctionDef]]:
    for room in NUMERIC:
        for path in sorted((ROOT / "models" / room).rglob("*.py")):
            for node in ast.parse(path.read_text()).body:
                if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
                    yield f"{path.relative_to(ROOT)}:{node.name}", node


@pytest.mark.parametrize(
    ("name", "node"), list(public_functions()), ids=lambda value: value if isinstance(value, str) else ""
)
def test_public_numeric_functions_are_documented(name: str, node: ast.FunctionDef) -> None:
    assert ast.get_docstring(node), name


@pytest.mark.parametrize("room", ["values", "decide", "estimate"])
def test_most_public_functions_have_an_executed_example(room: str) -> None:
    nodes = [node for name, node in public_functions() if name.startswith(f"models/{room}/")]
    with_example = [node.name for node in nodes if ">>>" in (ast.get_docstring(node) or "")]
    assert len(with_example) >= 0.5 * len(nodes), sorted({node.name for node in nodes} - set(with_example))
