from tideboard.feeds import read_all

rows = read_all()
