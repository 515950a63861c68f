"""The gas trade, over entries: pure folds and judgements, each with its reasons. Nothing here reads a clock."""
