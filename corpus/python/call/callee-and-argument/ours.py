async def warn(box, level):
    message = format_warning(level)
    await box.radio.transmit(message, urgent=False)
    box.flush()
