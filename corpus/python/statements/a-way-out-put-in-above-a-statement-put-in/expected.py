def draw(day):
    tide = fetch(day)

    if tide is None:
        report(day)

    margin = 2
    width = 40 - margin
    chart(tide, width)
