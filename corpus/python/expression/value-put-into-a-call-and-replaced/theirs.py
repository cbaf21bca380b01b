def stamp(match, form):
    when = None
    if match:
        when = datetime.strptime(match.group("when"), form)
        if ZONE:
            when = when.replace(tzinfo=ZONE)
    return when
