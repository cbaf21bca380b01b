def test_levels(board):
    rows = board.rows("kiel")
    assert list(rows.levels()) == [{1, 2, 3}, set()]
