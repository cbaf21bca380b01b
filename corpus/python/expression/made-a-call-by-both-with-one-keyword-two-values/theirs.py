@pytest.fixture(scope="session")
def board(tmp_path):
    return Board(tmp_path)
