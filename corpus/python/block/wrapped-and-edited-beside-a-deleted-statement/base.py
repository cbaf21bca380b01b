def publish(station):
    path = folder / f'{station}/forecast.zip'
    with archive(path, 'w') as out:
        for tide, height in forecast(folder / f'{station}'):
            name = 'forecast' / relative(tide.as_path())
            print(tide, '->', name)
            out.write(tide, name)
