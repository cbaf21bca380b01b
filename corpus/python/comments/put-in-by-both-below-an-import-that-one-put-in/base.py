import tideboard

def test_levels():
    assert tideboard.levels() == [1, 2]
