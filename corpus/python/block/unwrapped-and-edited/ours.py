def publish(chart, store):
    image = chart.render()
    store.put(image)
    return chart
