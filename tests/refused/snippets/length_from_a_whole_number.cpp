// says: conversion from .int. to non-scalar type .quoin::Mm.
#include "base/units.h"

using namespace quoin;

#ifdef REFUSED
Mm width = 63;
#else
Mm width = 63_mm;
#endif
