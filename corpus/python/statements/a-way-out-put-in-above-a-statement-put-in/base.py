def draw(day):
    tide = fetch(day)

    width = 40
    chart(tide, width)
