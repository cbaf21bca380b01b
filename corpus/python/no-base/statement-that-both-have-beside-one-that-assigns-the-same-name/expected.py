def test_len(self):
    board = self.board(self.port)
<<<<<<< ours
    rows = board(data='level')
    assert_raises(TypeError, len, rows)
=======
    rows = board()
    number = 9 if self.port.has_quays() else 8
    assert_equal(len(rows), number)
    rows = board(data='level')
    assert_equal(len(rows), number)
>>>>>>> theirs
