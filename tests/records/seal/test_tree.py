from hashlib import sha256

import pytest
from hypothesis import given
from hypothesis import strategies as st

from repairlog.records.seal import EMPTY, Frontier, from_bytes, grown, leaf, root, to_bytes
from tests.makers.sealed import tree_of


def defined_root(lines: list[bytes]) -> bytes:
    """MTH of RFC 9162 section 2.1.1, as it is defined: split at the largest power of two below the size."""
    if not lines:
        return sha256(b"").digest()
    if len(lines) == 1:
        return sha256(b"\x00" + lines[0]).digest()
    split = 1
    while split * 2 < len(lines):
        split *= 2
    return sha256(b"\x01" + defined_root(lines[:split]) + defined_root(lines[split:])).digest()


def numbered(size: int) -> list[bytes]:
    return [b"line %d" % index for index in range(size)]


def test_every_tree_of_up_to_300_lines_has_the_root_that_the_standard_defines() -> None:
    lines, tree = numbered(300), EMPTY
    assert root(tree) == defined_root([])
    for index, line in enumerate(lines):
        tree = grown(tree, [leaf(line)])
        assert (tree.size, root(tree)) == (index + 1, defined_root(lines[: index + 1]))


@given(st.lists(st.binary(max_size=4), max_size=40))
def test_a_tree_of_any_lines_has_the_root_that_the_standard_defines(lines: list[bytes]) -> None:
    assert root(tree_of(lines)) == defined_root(lines)


def test_the_peaks_are_the_roots_of_the_full_subtrees_largest_first() -> None:
    lines = numbered(13)
    assert tree_of(lines) == Frontier(
        size=13, peaks=(defined_root(lines[:8]), defined_root(lines[8:12]), defined_root(lines[12:]))
    )


@given(st.integers(min_value=0, max_value=300))
def test_a_stored_frontier_comes_back_and_is_carried_on(size: int) -> None:
    tree = tree_of(numbered(size))
    stored = from_bytes(tree.size, to_bytes(tree))
    assert stored == tree
    assert grown(stored, [leaf(b"next")]) == tree_of([*numbered(size), b"next"])


@given(st.integers(min_value=0, max_value=40), st.integers(min_value=0, max_value=40))
def test_a_tree_grown_by_many_leaves_at_once_is_the_same_tree(size: int, more: int) -> None:
    lines = numbered(size + more)
    assert grown(tree_of(lines[:size]), map(leaf, lines[size:])) == tree_of(lines)


def test_the_stored_bytes_are_the_peaks_in_a_row() -> None:
    lines = numbered(3)
    assert to_bytes(tree_of(lines)) == defined_root(lines[:2]) + leaf(lines[2])
    assert to_bytes(EMPTY) == b""
    assert from_bytes(0, b"") == EMPTY


@given(
    lines=st.lists(st.binary(min_size=1, max_size=6), min_size=1, max_size=20),
    chosen=st.data(),
)
def test_turning_any_bit_of_any_line_or_leaf_changes_the_root(lines: list[bytes], chosen: st.DataObject) -> None:
    index = chosen.draw(st.integers(min_value=0, max_value=len(lines) - 1))
    bit = chosen.draw(st.integers(min_value=0, max_value=len(lines[index]) * 8 - 1))
    turned = [*lines[:index], turn(lines[index], bit), *lines[index + 1 :]]
    assert root(tree_of(turned)) != root(tree_of(lines))
    leaves = [leaf(line) for line in lines]
    bit = chosen.draw(st.integers(min_value=0, max_value=255))
    turned = [*leaves[:index], turn(leaves[index], bit), *leaves[index + 1 :]]
    assert root(grown(EMPTY, turned)) != root(tree_of(lines))


def turn(data: bytes, bit: int) -> bytes:
    return (int.from_bytes(data) ^ 1 << bit).to_bytes(len(data))


def test_exchanging_two_lines_or_leaving_the_last_away_changes_the_root() -> None:
    lines = numbered(6)
    exchanged = [lines[1], lines[0], *lines[2:]]
    assert len({root(tree_of(those)) for those in (lines, exchanged, lines[:-1], [*lines, lines[-1]])}) == 4


def test_a_line_cannot_pass_for_a_node_over_two_others() -> None:
    # The second of the two leaves' digests joined as if they were one line: 00 and 01 keep the two apart.
    one, other = leaf(b"one"), leaf(b"other")
    assert root(tree_of([one + other])) != root(tree_of([b"one", b"other"]))


@pytest.mark.parametrize(("size", "wanted"), [(0, 0), (1, 1), (2, 1), (3, 2), (255, 8), (256, 1)])
def test_a_frontier_with_a_peak_too_few_or_too_many_is_refused(size: int, wanted: int) -> None:
    assert from_bytes(size, bytes(32 * wanted)) == Frontier(size=size, peaks=(bytes(32),) * wanted)
    for count in {wanted - 1, wanted + 1} - {-1}:
        with pytest.raises(ValueError, match=f"of {size} leaves has {wanted} peaks, one a binary one; {count} came"):
            from_bytes(size, bytes(32 * count))


@pytest.mark.parametrize("length", [31, 33])
def test_a_digest_of_another_length_is_refused(length: int) -> None:
    with pytest.raises(ValueError, match=f"digests of 32 bytes; {length} bytes came"):
        grown(EMPTY, [bytes(32), bytes(length), bytes(32)])
    with pytest.raises(ValueError, match="peaks"):
        from_bytes(3, bytes(32 + length + 32))


def test_a_stored_peak_cut_short_is_refused() -> None:
    with pytest.raises(ValueError, match="digests of 32 bytes; 31 bytes came"):
        from_bytes(3, bytes(63))


def test_a_tree_of_less_than_no_leaves_is_refused() -> None:
    with pytest.raises(ValueError, match="a tree has no -1 leaves"):
        from_bytes(-1, bytes(32))


@pytest.mark.parametrize(("before", "more"), [(0, 1023), (1, 1024), (5, 1025), (8, 2500), (1024, 1)])
def test_more_leaves_than_are_drawn_at_once_make_the_tree_that_the_standard_defines(before: int, more: int) -> None:
    lines = numbered(before + more)
    found = grown(tree_of(lines[:before]), (leaf(line) for line in lines[before:]))
    assert (found.size, root(found)) == (before + more, defined_root(lines))
