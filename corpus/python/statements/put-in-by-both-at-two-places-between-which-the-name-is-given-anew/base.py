def test_board():
    rows = {"kiel": {"kiel": 1, "husum": 2},
            "husum": {"kiel": 10, "husum": 20}}
    table = board(rows)
    assert_equal(table, array([[1, 2], [10, 20]]))
    rows = {"kiel": 1, "husum": 2}
    table = board1(rows)
    assert_equal(table, array([1, 2]))
