def publish(chart, store):
    if chart.ready:
        image = chart.render()
        store.put(image)
    return chart
