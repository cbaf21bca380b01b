def test_len(self):
    board = self.board(self.port)
    rows = board(data='level')
    assert_raises(TypeError, len, rows)
