def test_board():
    rows = {"kiel": {"kiel": 1, "husum": 2},
            "husum": {"kiel": 10, "husum": 20}}
    table = board(rows)
    assert_equal(table, array([[1, 2], [10, 20]]))
    rows = {"kiel": 1, "husum": 2}
    order = {"kiel": 0, "husum": 1}
    table = board1(rows, order=order)
    assert_equal(table, array([1, 2]))
