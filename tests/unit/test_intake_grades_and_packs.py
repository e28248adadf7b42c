"""Grades and counts of cases: what only the one who wrote the list knows is asked, and what was said is followed."""

import pytest

from models.intake.history import read_history
from models.intake.manifest import ReadManifest, read_manifest
from models.values.errors import NeedsColumns, Rejected
from models.values.questions import Question

GRADES = "Description,Qty,Unit Retail,Grade\nMug,1,5.00,A\nJug,3,9.00,B\nPot,1,3.00,grade c\nPan,1,3.00,New\n"
CASES = "Description,Cases,Case Pack,Unit Retail\nMug,1,12,6.00\nJug,3,6/case,19.00\n"


def read(text: str, **mapping: str) -> ReadManifest:
    return read_manifest(text.encode(), "load.csv", mapping, "USD")


def asked(text: str, **mapping: str) -> dict[str, Question]:
    with pytest.raises(NeedsColumns) as caught:
        read(text, **mapping)
    assert caught.value.missing == tuple(question.key for question in caught.value.questions)
    return {question.key: question for question in caught.value.questions}


def test_each_unknown_grade_is_asked_once() -> None:
    questions = asked(GRADES)
    assert list(questions) == ["condition:A", "condition:B", "condition:GRADE C"]
    assert [choice.value for choice in questions["condition:A"].choices] == [
        "sealed",
        "opened",
        "works",
        "worn",
        "untested",
        "salvage",
        "unknown",
    ]


def test_what_grades_mean_is_followed_and_the_files_own_words_are_kept() -> None:
    answers = {"condition:A": "sealed", "condition:B": "worn", "condition:GRADE C": "unknown"}
    done = read(GRADES, **answers)
    assert done.lines.condition.tolist() == [0, 3, -1, 0]
    assert done.lines.condition_said.tolist() == ["A", "B", "grade c", "New"]
    assert done.problems.items == ()
    assert answers.items() <= done.mapping.items()
    assert list(asked(GRADES, **{"condition:A": "sealed"})) == ["condition:B", "condition:GRADE C"]


def test_a_source_may_mean_something_else_by_words_we_know() -> None:
    done = read("Description,Qty,Condition\nMug,1,Good\nJug,1,good\n", **{"condition:GOOD": "untested"})
    assert done.lines.condition.tolist() == [4, 4]


def test_a_few_unknown_wordings_stay_unknown_and_are_named() -> None:
    done = read("Description,Qty,Condition\nMug,1,New\nJug,1,New\nPot,1,Used\nPan,1,Grade B\n")
    assert done.lines.condition.tolist() == [0, 0, 3, -1]
    assert [(item.row, item.value, item.done) for item in done.problems.items] == [(5, "Grade B", "taken as unknown")]


def test_wordings_that_are_no_grades_stay_unknown_without_a_question() -> None:
    done = read("Description,Qty,Condition\nMug,1,banana\nJug,1,lovely thing\nPot,1,90% new\n")
    assert done.lines.condition.tolist() == [-1] * 3
    assert [item.done for item in done.problems.items] == ["taken as unknown"] * 3
    assert read("Description,Condition\nMug,banana\n", **{"condition:BANANA": "worn"}).lines.condition.tolist() == [3]


@pytest.mark.parametrize("grade", ["A", "b+", "AA", "Grade C", "Class 2", "C-Stock", "B-Ware", "1000", "3", "Cond: D"])
def test_what_a_grade_looks_like(grade: str) -> None:
    assert list(asked(f"Description,Qty,Condition\nMug,1,{grade}\nJug,1,{grade}\n"))


def test_an_answer_that_is_no_condition_is_refused() -> None:
    with pytest.raises(Rejected, match="must be one of sealed"):
        read(GRADES, **{"condition:A": "fine"})


def test_cases_are_asked() -> None:
    question = asked(CASES)["quantity_is"]
    assert [choice.value for choice in question.choices] == ["units", "Case Pack"]
    assert question.number


@pytest.mark.parametrize(("answer", "units"), [("units", [1, 3]), ("24", [24, 72]), ("Case Pack", [12, 18])])
def test_what_was_said_of_cases_is_followed(answer: str, units: list[int]) -> None:
    done = read(CASES, quantity_is=answer)
    assert done.lines.quantity.tolist() == units
    assert (done.mapping["quantity"], done.mapping["quantity_is"]) == ("Cases", answer)


def test_an_answer_that_names_no_column_of_sizes_is_asked_again() -> None:
    assert "quantity_is" in asked(CASES, quantity_is="Unit Retail")


def test_cells_that_speak_of_cases_are_asked_and_a_few_are_only_named() -> None:
    assert "quantity_is" in asked("Description,Qty\nMug,4 CS\nJug,2 cases\nPot,1\n")
    done = read("Description,Qty\nMug,4 CS\nJug,2\nPot,1\n")
    assert done.lines.quantity.tolist() == [4, 2, 1]
    assert [item.reason for item in done.problems.items] == ["the quantity may count packs, not units"]


@pytest.mark.parametrize("header", ["Qty (units)", "Units", "Qty EA", "Pieces"])
def test_units_are_not_asked_about_although_a_case_size_stands_beside(header: str) -> None:
    done = read(f"Description,{header},Case Pack\nMug,24,12\nJug,3,6\n")
    assert done.lines.quantity.tolist() == [24, 3]


def test_a_case_size_that_cannot_be_read_sets_its_row_aside() -> None:
    done = read(CASES + "Pot,2,some,3.00\n", quantity_is="Case Pack")
    assert (done.problems.rows, done.problems.kept) == (3, 2)
    assert [(item.row, item.column, item.done) for item in done.problems.items] == [(4, "Case Pack", "set aside")]


def test_assorted_goods_and_rows_of_one_unit_each() -> None:
    done = read("Description|Qty|Unit Retail\nAsst knit tops 24M-5T|96|9.99\nPolo|1|20\n")
    assert (done.lines.quantity.tolist(), done.lines.assorted.tolist()) == ([96, 1], [True, False])
    forty = read("Description,Qty,SKU\n" + "Blue mug,1,M-1\n" * 40)
    assert (len(forty.lines), set(forty.lines.quantity.tolist())) == (40, {1})


def test_a_sellers_own_grades_in_a_history_are_asked_and_followed() -> None:
    text = "Title,Sold for,Grade,Date sold\nMug,5.00,A,2026-05-01\nJug,9.00,B,2026-05-02\n"
    with pytest.raises(NeedsColumns) as caught:
        read_history(text.encode(), "s.csv", {}, "USD")
    assert caught.value.missing == ("condition:A", "condition:B")
    answers = {"condition:A": "sealed", "condition:B": "works"}
    assert read_history(text.encode(), "s.csv", answers, "USD").sales.condition.tolist() == [0, 2]
