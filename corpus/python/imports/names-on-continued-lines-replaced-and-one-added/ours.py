from gauges import beam,\
     eel,\
     oak,\
     ash
