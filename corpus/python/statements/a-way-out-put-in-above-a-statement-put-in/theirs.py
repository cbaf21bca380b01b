def draw(day):
    tide = fetch(day)

    if tide is None:
        report(day)

    width = 40
    chart(tide, width)
