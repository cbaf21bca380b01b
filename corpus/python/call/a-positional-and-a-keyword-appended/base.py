for port in ports:
    row = lookup(port)
    table.append(row)
