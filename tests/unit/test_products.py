"""Products: any shared key joins, names do not depend on the order of rows."""

import numpy as np

from models.estimate.products import build_book, item_name, match
from models.values.arrays import texts


def _none(n: int):
    return texts([""] * n)


def test_the_same_gtin_is_one_product_whatever_the_words_say():
    book, product = build_book(texts(["Red mug", "Mug crimson"]), _none(2), texts(["4006381333931"] * 2))
    assert product.tolist() == [0, 0]
    assert book.n_products == 1


def test_the_same_words_are_one_product_whatever_their_order_and_punctuation():
    _, product = build_book(texts(["Kettle, STEEL 1.7L", "steel kettle (1,7l)", "steel kettle"]), _none(3), _none(3))
    assert product[0] == product[1] != product[2]


def test_a_sku_joins_only_with_the_same_words():
    _, product = build_book(texts(["red mug", "blue mug"]), texts(["A1", "A1"]), _none(2))
    assert product[0] != product[1]


def test_keys_join_through_a_chain():
    _, product = build_book(
        texts(["red mug", "red mug", "mug nr 7"]), _none(3), texts(["", "4006381333931", "4006381333931"])
    )
    assert len(set(product.tolist())) == 1


def test_titles_without_a_word_are_told_apart_by_their_signs():
    _, product = build_book(texts(["???", "!!!", "???"]), _none(3), _none(3))
    assert product[0] == product[2] != product[1]


def test_a_line_is_matched_by_any_key_and_new_lines_group_among_themselves():
    book, _ = build_book(texts(["red mug", "plate"]), _none(2), texts(["4006381333931", ""]))
    found = match(book, texts(["odd words", "Plate", "new thing", "thing new", "other"]), _none(5),
                  texts(["4006381333931", "", "", "", ""]))  # fmt: skip
    assert found.known.tolist() == [True, True, False, False, False]
    assert found.product[2] == found.product[3] != found.product[4]
    assert min(found.product[2:]) >= book.n_products
    assert found.name[0] == book.name[found.product[0]]


def test_a_line_without_a_known_key_takes_the_product_of_a_line_it_shares_one_with():
    book, _ = build_book(texts(["red mug"]), _none(1), _none(1))
    found = match(book, texts(["red mug", "crimson cup"]), _none(2), texts(["4006381333931"] * 2))
    assert found.product.tolist() == [0, 0]


def test_names_do_not_depend_on_the_order_of_rows():
    title = texts(["red mug", "plate", "mug red big", "bowl", "plate"])
    gtin = texts(["4006381333931", "", "4006381333931", "", "96385074"])
    book, _ = build_book(title, _none(5), gtin)
    order = np.array([3, 1, 4, 0, 2])
    other, _ = build_book(title[order], _none(5), gtin[order])
    assert book.name.tolist() == other.name.tolist()
    assert book.key.tolist() == other.key.tolist()
    lines = texts(["new b", "plate", "new a", "b new"])
    first, second = match(book, lines, _none(4), _none(4)), match(book, lines[::-1], _none(4), _none(4))
    assert first.name.tolist() == second.name[::-1].tolist()
    assert first.product.tolist() == second.product[::-1].tolist()


def test_an_empty_history_has_an_empty_book():
    book, product = build_book(_none(0), _none(0), _none(0))
    assert (book.n_products, len(product)) == (0, 0)
    assert match(book, texts(["a"]), _none(1), _none(1)).known.tolist() == [False]


def test_an_item_is_a_product_in_one_condition():
    assert item_name("w:a", 0) != item_name("w:a", 1)


def test_one_gtin_is_one_product_whatever_length_it_is_written_in() -> None:
    book, product = build_book(texts(["a mug", "cup"]), texts(["", ""]), texts(["036000291452", "0036000291452"]))
    assert book.n_products == 1
    assert product.tolist() == [0, 0]
