module musette

go 1.26.0
