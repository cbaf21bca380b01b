for row in rows:
<<<<<<< ours
    print(f"{row.port}: {row.height:.1f} m")
=======
    print(f"{row.port.name}: {row.height} m")
>>>>>>> theirs
