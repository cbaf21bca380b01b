@pytest.fixture(autouse=True)
def board(tmp_path):
    return Board(tmp_path)
