def main():
    serve(make_app(debug=False), port=8080, host="0.0.0.0")
