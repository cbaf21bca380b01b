def main():
    serve(make_app(debug=False), port=8080)
