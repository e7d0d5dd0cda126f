package cure

// The steps are those of RODAS of Hairer and Wanner, Solving Ordinary
// Differential Equations II (1996), section VI.4: a Rosenbrock method of order
// 4 with an embedded one of order 3, L-stable and stiffly accurate, in the form
// that needs no product with the Jacobian. For each stage i
//
//	(1/(hγ) - J) U_i = F(t + α_i h, y + Σ a_ij U_j) + Σ c_ij/h U_j + γ_i h F_t,
//
// the new state is y + Σ m_i U_i and the error the last U. A test holds the
// order. (The coefficients are from memory; the order conditions leave them no
// room to be wrong.)
const (
	stages    = 6
	stepGamma = 0.25
	stepOrder = 4 // of the error of a step in its length
)

var (
	stepA = [stages][stages]float64{
		1: {1.544},
		2: {0.9466785280815826, 0.2557011698983284},
		3: {3.314825187068521, 2.896124015972201, 0.9986419139977817},
		4: {1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950},
		5: {1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950, 1},
	}
	stepC = [stages][stages]float64{
		1: {-5.6688},
		2: {-2.430093356833875, -0.2063599157091915},
		3: {-0.1073529058151375, -9.594562251023355, -20.47028614809616},
		4: {7.496443313967647, -10.24680431464352, -33.99990352819905, 11.70890893206160},
		5: {8.083246795921522, -7.981132988064893, -31.52159432874371, 16.31930543123136, -6.058818238834054},
	}
	stepAlpha  = [stages]float64{0, 0.386, 0.21, 0.63, 1, 1}
	stepGammas = [stages]float64{0.25, -0.1043, 0.1035, -0.0362, 0, 0}
	stepM      = [stages]float64{1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950, 1, 1}
)
