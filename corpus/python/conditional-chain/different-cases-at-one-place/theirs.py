def draw(kind, row):
    match kind:
        case "high":
            draw_high(row, bold=True)
        case "slack":
            draw_slack(row)
        case _:
            skip(row)
