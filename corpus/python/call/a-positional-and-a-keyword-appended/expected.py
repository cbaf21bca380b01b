for port in ports:
    row = lookup(port, today, unit="ft")
    table.append(row)
