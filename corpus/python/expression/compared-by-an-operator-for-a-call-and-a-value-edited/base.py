def test_levels(board):
    rows = board.rows("kiel")
    assert_equal(list(rows.levels()), [set([1, 2, 3]), set([])])
