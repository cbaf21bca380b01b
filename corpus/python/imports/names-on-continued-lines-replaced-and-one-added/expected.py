from gauges import \
     oak,\
     fir,\
     gorse,\
     ivy,\
     ash
