for port in ports:
    row = lookup(port, unit="ft")
    table.append(row)
