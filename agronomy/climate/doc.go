// Package climate holds the arithmetic of weather records and of weather ahead: how a gap is filled
// from neighbours, how like this season a past one was, how a forecast and the climate are weighed
// against each other, how days are made where a record is short, and how a forecast is scored
// afterwards. It knows numbers only; package weather lays them over stations and days.
package climate
