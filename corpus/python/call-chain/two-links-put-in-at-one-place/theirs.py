qs = q.filter(s).distinct().order_by("time")
