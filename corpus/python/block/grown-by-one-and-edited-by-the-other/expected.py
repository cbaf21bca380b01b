if True:

    def plot_day(readings):
        """Draws one day."""
        for time, level in readings:
            canvas.dot(time, level)
            canvas.line(time, 0, time, level)
            if level > storm_level:
                canvas.flag(time, level, colour="red")
            lowest = min(lowest, level)
            highest = max(highest, level)
            note = describe(time, level, lowest, highest)
            canvas.label(time, level, note, size=8)
        assert canvas.dots == len(readings)
