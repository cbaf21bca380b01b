from gauges import beam,\
     eel,\
     ash
