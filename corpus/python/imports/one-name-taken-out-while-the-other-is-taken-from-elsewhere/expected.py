from harbour.sources import read_all

rows = read_all()
