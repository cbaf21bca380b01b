for port in ports:
    row = lookup(port, today)
    table.append(row)
