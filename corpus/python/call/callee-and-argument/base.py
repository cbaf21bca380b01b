async def warn(box, level):
    message = format_warning(level)
    await box.send(message, urgent=False)
    box.flush()
