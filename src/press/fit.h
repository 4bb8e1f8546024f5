#pragma once
#include <array>
#include <optional>
#include <vector>

#include "geometry/geometry.h"

namespace quoin::press {

/// A place as it was meant, and where it was found.
struct Pair {
  Point meant, found;
};

/// The map that takes what was meant nearest to what was found, in the sense of least squares, and
/// how far it can be trusted.
struct AffineFit {
  Affine map;
  std::vector<bool> kept;  ///< one for each pair: false for those rejected as outliers
  int used = 0;            ///< pairs that were kept
  Mm rms;                  ///< of the kept pairs' distances from the map
  Mm deviation;            ///< standard error of one coordinate of one place: sqrt(SS / (2n - 6))
  /// Inverse of the normal matrix of (1, x, y) about `centre`, row after row, x and y in mm.
  std::array<double, 9> spread{};
  Point centre;  ///< of the kept places as meant

  /// The standard error of one coordinate of the mapped place: deviation · sqrt(u' (A'A)^-1 u).
  [[nodiscard]] Mm error_at(Point meant) const;
};

/// How outliers are told: those farther off than three times the median distance (made comparable
/// to a standard deviation by 1.4826) and than `floor` are left out and the rest fitted again.
struct Rejection {
  Mm floor{0.05};
};

/// Fits x' = a·x + c·y + e, y' = b·x + d·y + f. Nothing with fewer than three pairs, or when they
/// lie on one line. With exactly three the fit is exact and says nothing of its errors: deviation
/// 0.
[[nodiscard]] std::optional<AffineFit> fit_affine(const std::vector<Pair>& pairs,
                                                  Rejection rejection = {});

/// Which similarity is asked for: size kept, or one scale for both ways.
enum class Scaling { none, free };

/// The turn, scale and move that take what was meant nearest to what was found, never a mirror
/// image.
///
/// S. Umeyama, "Least-squares estimation of transformation parameters between two point patterns",
/// IEEE Trans. Pattern Analysis and Machine Intelligence 13(4), 1991, eqs. (40) to (43); in the
/// plane the turn is atan2 of the sums of cross and dot products, which is the same for det R = 1.
/// Nothing with fewer than two different places.
struct Similarity {
  Affine map;
  Angle turn;
  double scale = 1;
  double mean_square = 0;  ///< mm²: mean of the squared distances that are left
};
[[nodiscard]] std::optional<Similarity> fit_similarity(const std::vector<Pair>& pairs,
                                                       Scaling scaling);

/// What an affine map does to a sheet, in words a person can check: about `centre`.
struct Parts {
  Vec shift;   ///< of the centre
  Angle turn;  ///< of the x axis, clockwise
  double scale_x = 1, scale_y = 1;
  Angle skew;  ///< how far the angle between the axes is off a right one
};
[[nodiscard]] Parts parts_of(const Affine& map, Point centre);

/// The bound that the map's error keeps to at the worst of the corners with 95 in 100: the error of
/// a place in two coordinates, by Hotelling's T² with 2 and 2(n-3) degrees of freedom as found from
/// the residuals, and never below `least` for one coordinate.
///
/// For the two coordinates of a place fitted with one common deviation, |error|²/(2·s²·h) follows
/// F(2, 2n-6) (e.g. Rencher, "Methods of Multivariate Analysis", ch. 5; from memory), whose 95 %
/// point for 2 and m degrees is m/2·(0.05^(-2/m) - 1): exact, since F(2, m) has a closed form.
/// A fit without residual freedom (three pairs) has no bound: nothing.
[[nodiscard]] std::optional<Mm> bound(const AffineFit& fit, const std::vector<Point>& corners,
                                      Mm least);

}  // namespace quoin::press
