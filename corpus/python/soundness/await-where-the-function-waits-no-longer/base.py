async def refresh(gauge):
    level = await gauge.read()
    store(level)

    chart = draw(level)
    publish(chart)

    log("refreshed")
