@pytest.fixture(scope="module")
def board(tmp_path):
    return Board(tmp_path)
