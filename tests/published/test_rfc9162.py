"""The tree over the sealed lines against published values of RFC 9162 (the tree of RFC 6962).

Sources of the values stand in the head of each file: the Certificate Transparency reference tree of eight leaves
(the root of size 4 from memory; those of sizes 1, 2, 3, 5, 6, 7 and 8 stand in the second file too), and the test data
of transparency-dev/merkle.
"""

from typing import Any

import pytest

from repairlog.records.seal import EMPTY, grown, leaf, node, root
from tests.makers.published import values
from tests.makers.sealed import tree_of

REFERENCE = values("merkle_rfc6962.json")
TRANSPARENCY_DEV = values("merkle_transparency_dev_vectors.json")
LEAVES = [bytes.fromhex(text) for text in REFERENCE["leaves_hex"]]


def root_by_path(digest: bytes, *, index: int, size: int, path: list[bytes]) -> bytes:
    """What a proof of inclusion leads to. Source: RFC 9162 section 2.1.3.2, step by step."""
    place, last = index, size - 1
    for beside in path:
        assert last > 0
        if place & 1 or place == last:
            digest = node(beside, digest)
            while place & 1 == 0 and place:
                place, last = place >> 1, last >> 1
        else:
            digest = node(digest, beside)
        place, last = place >> 1, last >> 1
    assert last == 0
    return digest


def test_leaf_node_and_the_tree_without_leaves_are_hashed_as_published() -> None:
    assert {
        "empty": root(EMPTY).hex(),
        "empty_leaf": leaf(b"").hex(),
        "leaf": leaf(b"L123456").hex(),
        "node": node(b"N123", b"N456").hex(),
    } == REFERENCE["published_hasher"]


def test_the_root_of_every_size_from_none_to_eight_is_the_published_one() -> None:
    roots = [root(tree_of(LEAVES[:size])).hex() for size in range(9)]
    assert roots == [REFERENCE["empty_root"], *REFERENCE["roots"]]


@pytest.mark.parametrize("case", TRANSPARENCY_DEV["consistency"], ids=lambda case: case["file"])
def test_both_roots_of_a_published_consistency_case_are_found(case: dict[str, Any]) -> None:
    earlier, later = tree_of(LEAVES[: case["size1"]]), tree_of(LEAVES[: case["size2"]])
    assert (root(earlier).hex(), root(later).hex()) == (case["root1"], case["root2"])
    assert grown(earlier, map(leaf, LEAVES[case["size1"] : case["size2"]])) == later


@pytest.mark.parametrize("case", TRANSPARENCY_DEV["inclusion"], ids=lambda case: case["file"])
def test_a_published_inclusion_proof_leads_from_our_leaf_to_our_root(case: dict[str, Any]) -> None:
    own = leaf(LEAVES[case["leafIdx"]])
    assert own.hex() == case["leafHash"]
    path = [bytes.fromhex(text) for text in case["proof"]]
    found = root_by_path(own, index=case["leafIdx"], size=case["treeSize"], path=path)
    assert found.hex() == root(tree_of(LEAVES[: case["treeSize"]])).hex() == case["root"]


def test_every_reference_inclusion_path_leads_to_our_root() -> None:
    found = [
        root_by_path(
            leaf(LEAVES[case["index"]]),
            index=case["index"],
            size=case["size"],
            path=[bytes.fromhex(text) for text in case["path"]],
        )
        for case in REFERENCE["inclusion"]
    ]
    assert len(found) == 36
    assert found == [root(tree_of(LEAVES[: case["size"]])) for case in REFERENCE["inclusion"]]
