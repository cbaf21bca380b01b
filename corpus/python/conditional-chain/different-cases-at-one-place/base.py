def draw(kind, row):
    match kind:
        case "high":
            draw_high(row)
        case _:
            skip(row)
