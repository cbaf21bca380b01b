def test_levels(board):
    rows = board.rows("kiel")
    assert_equal(list(rows.levels()), [{1, 2, 3}, set()])
