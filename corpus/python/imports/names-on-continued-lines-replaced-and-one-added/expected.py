from gauges import \
     fir,\
     gorse,\
     ivy,\
     oak,\
     ash
