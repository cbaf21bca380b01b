<<<<<<< ours
def refresh(gauge):
    level = gauge.read()
    store(level)

    chart = draw(level)
    publish(chart)

=======
async def refresh(gauge):
    level = await gauge.read()
    store(level)

    chart = draw(level)
    publish(chart)

    await board.show(chart)
>>>>>>> theirs
    log("refreshed")
