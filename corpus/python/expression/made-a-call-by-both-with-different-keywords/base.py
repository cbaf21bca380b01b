@pytest.fixture
def board(tmp_path):
    return Board(tmp_path)
