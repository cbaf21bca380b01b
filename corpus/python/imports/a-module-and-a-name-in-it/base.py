import tides

print(tides.high())
