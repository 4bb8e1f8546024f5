// says: conversion from .double. to non-scalar type .quoin::Mm.
#include "base/units.h"

using namespace quoin;

#ifdef REFUSED
Mm width = 63.5;
#else
Mm width = Mm{63.5};
#endif
