<<<<<<< ours
@pytest.fixture(scope="module")
=======
@pytest.fixture(scope="session")
>>>>>>> theirs
def board(tmp_path):
    return Board(tmp_path)
