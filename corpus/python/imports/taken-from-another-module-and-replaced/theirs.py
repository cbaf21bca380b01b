from tideboard import Port

rows = 1
