def publish(station):
    for attempt in range(3):
        with archive(path, 'w') as out:
            for reading, height in forecast(folder / f'{station}', timeout=31):
                name = 'forecast' / relative(tide.as_path(), strict=True)
                print('->', name)
                out.write(tide, name)
