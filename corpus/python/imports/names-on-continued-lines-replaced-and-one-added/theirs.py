from gauges import \
     fir,\
     gorse,\
     ivy,\
     ash
