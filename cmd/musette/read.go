package main

import (
	"context"
	"errors"
	"io"
	"os"
)

// maxFile is the largest file of an operator or a rider that is read, in bytes.
const maxFile = 1 << 20

var (
	errTooLarge    = errors.New("is larger than 1 MiB")
	errStopped     = errors.New("interrupted. Run it again, since a part of it may be done")
	errInterrupted = errors.New("interrupted before all of the input was there. Nothing was done")
)

// readFile reads a file of at most maxFile bytes. A pipe may wait for somebody
// who never writes, so an interrupt ends it.
func readFile(ctx context.Context, path string) ([]byte, error) {
	return unlessInterrupted(ctx, func() ([]byte, error) {
		file, err := os.Open(path)
		if err != nil {
			return nil, err
		}
		defer file.Close() //nolint:errcheck // only read
		return readBounded(file)
	})
}

// readInput is readFile of an open stream.
func readInput(ctx context.Context, in io.Reader) ([]byte, error) {
	return unlessInterrupted(ctx, func() ([]byte, error) { return readBounded(in) })
}

func readBounded(in io.Reader) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(in, maxFile+1))
	if err == nil && len(data) > maxFile {
		err = errTooLarge
	}
	return data, err
}

// unlessInterrupted gives up waiting when ctx ends; the read itself ends with the program.
func unlessInterrupted(ctx context.Context, read func() ([]byte, error)) ([]byte, error) {
	type result struct {
		data []byte
		err  error
	}
	done := make(chan result, 1)
	go func() {
		data, err := read()
		done <- result{data, err}
	}()
	select {
	case <-ctx.Done():
		return nil, errInterrupted
	case r := <-done:
		return r.data, r.err
	}
}
