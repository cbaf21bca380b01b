def draw(kind, row):
    match kind:
        case "high":
            draw_high(row)
        case "low":
            draw_low(row)
        case _:
            skip(row)
