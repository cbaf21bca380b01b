def publish(station):
    with archive(path, 'w') as out:
        for reading, height in forecast(folder / f'{station}'):
            name = 'forecast' / relative(tide.as_path())
            print('->', name)
            out.write(tide, name)
