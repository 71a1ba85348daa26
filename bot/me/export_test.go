package me

var EntryWords = entryWords
