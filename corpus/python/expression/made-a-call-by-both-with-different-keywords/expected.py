@pytest.fixture(autouse=True, name="board_fixture")
def board(tmp_path):
    return Board(tmp_path / "b")
