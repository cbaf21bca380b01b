if True:

    def plot_day(readings):
        """Draws one day."""
        for time, level in readings:
            canvas.dot(time, level)
