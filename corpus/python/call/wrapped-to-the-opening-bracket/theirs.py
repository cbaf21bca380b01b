record = parse_line(line, station=code, strict=True, unit=unit)
records.append(record)
