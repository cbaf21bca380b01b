for row in rows:
    print(f"{row.port}: {row.height} m")
