def publish(chart, store):
    image = chart.render()
    store.put(image, public=True)
    return chart
