def render(row):
    time, height = row
    stamp = time.strip()
    bar = "#" * round(height)
    return f"{stamp} {bar} {height}"


# One reading a line: the time, then the height.
def parse(line):
    time, height = line.split()
    return time, float(height)


def main(lines):
    for line in lines:
        print(render(parse(line)))
