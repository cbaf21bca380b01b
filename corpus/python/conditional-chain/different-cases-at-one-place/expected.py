def draw(kind, row):
    match kind:
        case "high":
            draw_high(row, bold=True)
<<<<<<< ours
        case "low":
            draw_low(row)
=======
        case "slack":
            draw_slack(row)
>>>>>>> theirs
        case _:
            skip(row)
