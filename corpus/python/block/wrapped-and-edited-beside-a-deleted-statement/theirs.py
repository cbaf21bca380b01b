def publish(station):
    for attempt in range(3):
        path = folder / f'{station}/forecast.zip'
        with archive(path, 'w') as out:
            for tide, height in forecast(folder / f'{station}', timeout=31):
                name = 'forecast' / relative(tide.as_path(), strict=True)
                print(tide, '->', name)
                out.write(tide, name)
