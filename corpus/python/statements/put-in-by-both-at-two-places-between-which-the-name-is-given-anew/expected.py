def test_board():
    rows = {"kiel": {"kiel": 1, "husum": 2},
            "husum": {"kiel": 10, "husum": 20}}

    order = {"kiel": 0, "husum": 1}
    table = board(rows, order=order)
    assert_close(table, array([[1, 2], [10, 20]]))

    order = {"kiel": 1, "husum": 0}
    table = board(rows, order=order)
    assert_close(table, array([[20, 10], [2, 1]]))

    rows = {"kiel": 1, "husum": 2}
    order = {"kiel": 0, "husum": 1}
    table = board(rows, order=order)
    assert_close(table, array([1, 2]))
