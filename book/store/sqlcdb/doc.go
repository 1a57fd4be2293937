// Package sqlcdb holds the queries of the book, made by sqlc from ../queries; only package store uses it.
package sqlcdb
