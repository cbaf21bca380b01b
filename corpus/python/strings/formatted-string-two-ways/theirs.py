for row in rows:
    print(f"{row.port.name}: {row.height} m")
