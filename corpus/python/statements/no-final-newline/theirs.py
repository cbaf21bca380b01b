import sys

print(sys.argv)
sys.exit(main())