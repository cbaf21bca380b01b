def draw(day):
    tide = fetch(day)

    margin = 2
    width = 40 - margin
    chart(tide, width)
