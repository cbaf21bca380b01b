qs = q.filter(s).exclude(bad=1).order_by("time")
