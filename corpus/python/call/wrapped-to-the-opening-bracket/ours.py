record = parse_line(line,
                    station=code,
                    strict=True)
records.append(record)
